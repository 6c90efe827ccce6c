"""What sheets state, so that two that disagree can be found."""
