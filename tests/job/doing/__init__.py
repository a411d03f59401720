"""What is turned and welded, bolt by bolt and run by run."""
