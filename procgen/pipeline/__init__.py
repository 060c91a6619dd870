"""The one place that knows the order of the stages and the gates between them."""

RULES: tuple[tuple[str, str, str], ...] = (
    ("no-plan", "error", "a station works a hold for which no procedure can be derived"),
    (
        "loaded-without-restraint",
        "error",
        "a unit is loaded where, with what is out of service, nothing holds it in some direction",
    ),
)
"""Rules that only the order of stages can see: name, severity, meaning."""
