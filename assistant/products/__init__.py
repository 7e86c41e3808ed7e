"""Product cards: what the bag in the installer's hand allows."""
