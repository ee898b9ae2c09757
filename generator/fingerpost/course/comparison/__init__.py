"""Two courses compared as models, never as texts: what changed for the player, how far it reaches, what did not."""
