"""What goes on screen: the only layer that knows Jupyter. `kit` holds the pieces pages are made of."""
