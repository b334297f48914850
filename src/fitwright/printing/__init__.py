"""How a mesh lies on a printer's bed: what fits, what hangs in the air, what it stands on, what it takes."""
