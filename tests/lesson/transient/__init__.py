"""How charging and discharging is taught."""
