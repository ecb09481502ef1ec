"""Installations: the shelf of jobs, decisions taken and stored, and what they show."""
