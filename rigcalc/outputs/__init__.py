"""What goes on paper or to other programs."""
