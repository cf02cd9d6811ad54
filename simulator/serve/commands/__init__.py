"""What follows ``benchcall`` on the command line, one file a command."""
