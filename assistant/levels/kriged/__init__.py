"""Parts of the surface with its uncertainty; :mod:`assistant.levels.kriging` is the way in."""
