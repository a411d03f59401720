"""What axles carry."""
