"""The site: air, slab and moisture, the rules they are held against, and who decides."""
