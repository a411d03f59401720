"""What is said of an entry before it is recorded: what it is about, what it unsettles, what it leaves open."""
