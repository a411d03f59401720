"""The pictures of a step: which there are, and the page that shows one of them."""
