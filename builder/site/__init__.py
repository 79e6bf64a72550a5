"""A lesson becomes pages: markup, templates, styles, scripts and fonts."""
