"""The mechanics of a blade in its guides, moved by an air cylinder: plain numbers in, plain numbers out."""
