"""What several topics share: refusals, threads, grades, tables, named sets."""
