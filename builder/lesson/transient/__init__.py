"""How charging and discharging through resistors is taught."""
