"""Published constants as YAML, each with its source and how it was checked."""
