"""The edge: what is read from disk, be it the writer's folder or what travels with the package."""
