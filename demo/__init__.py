"""One whole job in an invented place, as typed lines and product cards."""
