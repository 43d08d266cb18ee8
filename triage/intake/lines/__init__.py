"""Lines cut into rows and cells, and where codes and names stand in them."""
