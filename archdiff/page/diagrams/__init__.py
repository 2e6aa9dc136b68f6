"""Pictures of the page: aligned block diagrams, board plans and strips."""
