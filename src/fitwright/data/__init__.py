"""Tables of standards and trade sizes, one CSV a standard, and the few functions that read them."""
