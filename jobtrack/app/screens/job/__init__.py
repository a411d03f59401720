"""The screens of one open job."""
