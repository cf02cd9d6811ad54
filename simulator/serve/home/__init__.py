"""Pages that need no kernel: the home page, the door to a call, paper to print."""
