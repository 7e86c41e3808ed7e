"""A page that shows the pour as it goes, for whoever runs the mixer: it is looked at, not told."""
