"""The pour plan page: lines, pots, what it comes to, and what to know before pouring."""
