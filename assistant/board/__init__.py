"""A page that shows the pour as it goes, for whoever runs the mixer, and one to talk to it from."""
