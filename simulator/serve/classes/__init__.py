"""What is known of a class, and what it asks of a visit."""
