"""From a build file with problems to one with fewer: edits are shown, chosen, and written all at once."""
