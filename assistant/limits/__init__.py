"""Each limit once, with its value, unit and source; and the usual cautions."""
