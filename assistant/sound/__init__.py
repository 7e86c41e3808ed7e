"""Sound: devices, files, rates and levels; and the packages that they need."""
