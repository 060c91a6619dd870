"""Where the published site is found, and the square code of an address for paper."""

from __future__ import annotations

import segno

from procgen.diagnostics import ProcgenError

_SCHEMES = ("https://", "http://")


def checked_address(text: str) -> str:
    """The address of a site without its last slash; nothing stands for no address.

    Raises `ProcgenError` for what a phone could not open.
    """
    address = text.strip().rstrip("/")
    if not address:
        return ""
    host = next((address.removeprefix(s) for s in _SCHEMES if address.startswith(s)), "")
    if not host or any(c.isspace() or c in '#?"<>' for c in address):
        raise ProcgenError(f"“{text}” is no address of a site: write it as https://manuals.example/holds")
    return address


def card_address(base: str, station: str, name: str) -> str:
    """The stable address of a card; nothing without a base."""
    return f"{base}/{station}/cards/{name}.html" if base else ""


def square_code(address: str) -> str:
    """The address as a QR code (ISO/IEC 18004, by the library segno), as SVG; nothing for no address."""
    if not address:
        return ""
    code = segno.make(address, error="m", micro=False)
    return code.svg_inline(scale=1, border=4, omitsize=True, svgclass=None, lineclass=None, dark="#000")
