"""What the services ask of the tables; each function takes the caller's session."""
