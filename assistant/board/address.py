"""Where a board may be reached."""

from __future__ import annotations

from assistant.errors import LeadsmanError

PORT = 8090
LOOPBACK = "127.0.0.1"


def own_address() -> str:
    """
    This machine's address on its network.

    Raises LeadsmanError where it has none that only a network of its own reaches.
    """
    import ipaddress
    import socket

    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: it only asks the system which way it would go.
            probe.connect(("192.0.2.1", 9))
            found = str(probe.getsockname()[0])
        except OSError as fault:
            raise LeadsmanError("This machine is on no network now; without --lan the board is on "
                                "this machine alone.") from fault  # fmt: skip
    if not ipaddress.ip_address(found).is_private or found.startswith("127."):
        raise LeadsmanError(
            f"This machine's address is {found}, which the whole internet may reach; a board is "
            "for a network of one's own. Without --lan it is on this machine alone."
        )
    return found


def code_lines(address: str) -> str:
    """An address as a code that a phone's camera takes, in half-blocks for a terminal."""
    import io

    import segno

    drawn = io.StringIO()
    segno.make(address, error="m").terminal(out=drawn, compact=True)
    return drawn.getvalue()
