"""What a table or text looks like, and its rows in the form that our own tables have."""
