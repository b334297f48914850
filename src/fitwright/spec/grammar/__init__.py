"""What the YAML says: a pydantic model for each map, a type for each value. The JSON Schema comes from these."""
