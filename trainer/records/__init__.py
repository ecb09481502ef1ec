"""What is kept: tables, sessions, queries and migrations. No Flask; plain values in and out."""
