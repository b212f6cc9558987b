"""The person who follows a cycle: bests, bar and discs, days."""
