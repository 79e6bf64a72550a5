"""Generated questions on circuits whose switches change: charging, and stage by stage."""
