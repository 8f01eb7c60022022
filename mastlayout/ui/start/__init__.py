"""The start page: six questions, the examples, the last layouts."""
