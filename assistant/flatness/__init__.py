"""What readings say of a floor's flatness and levelness, and how surely: plain numbers."""
