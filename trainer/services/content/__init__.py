"""What makes the content of a family good, measured: words, guesses, margins, likeness, counts."""
