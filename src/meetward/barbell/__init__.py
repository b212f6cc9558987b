"""The bar and its discs: what can be loaded, with which discs, and the way up to the first work set."""
