"""The bodies of a gate bracket, each from the one plan of its numbers."""
