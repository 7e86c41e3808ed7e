"""The site: air, slab and moisture, and the rules of what stands against pouring."""
