"""The hose hanger: profile, mounts, bodies."""
