"""How long things take on this computer: pages, answers, solutions."""
