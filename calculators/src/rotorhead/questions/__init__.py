"""Questions computed for any head from a seed: beliefs, templates, marking, papers. Fetched only where somebody asks
(scripts/site/parts.py)."""
