"""Files of points, of a total station, a scanner or a laser: read whole, or refused by the row."""
