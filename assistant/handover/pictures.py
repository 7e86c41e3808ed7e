"""Pictures as files: SVG, and PNG made from it."""

from __future__ import annotations

from assistant.handover.extras import needed
from assistant.handover.picture.plan import plan_svg
from assistant.handover.picture.profile import profile_svg
from assistant.handover.picture.views import view_of
from assistant.job import Job

_PAGE = """\
#set page(width: auto, height: auto, margin: 0pt, fill: white)
#image(bytes(sys.inputs.svg), format: "svg", width: 640pt)
"""
_DOTS_AN_INCH = 144


def picture_of(
    job: Job, name: str, show: str = "", along: tuple[str, str] | None = None
) -> tuple[str, str]:
    """
    A picture, and the name of its file without ending.

    Parameters
    ----------
    job, name
    show : str
        What of the floor, as ``views.VIEWS``; nothing for what was poured, or is to be.
    along : two points, optional
        A cut from one to the other instead.
    """
    if along is not None:
        return profile_svg(job, name, *along), f"cut-{along[0]}-{along[1]}"
    return plan_svg(job, name, show), view_of(job, show).name


def as_png(svg: str) -> bytes:
    """A picture in dots; LeadsmanError where typst, which draws them, is not installed."""
    with needed("A picture in PNG", "report"):
        import typst

    found = typst.Compiler(
        _PAGE.encode(), ignore_system_fonts=True, sys_inputs={"svg": svg}
    ).compile(format="png", ppi=_DOTS_AN_INCH)
    assert isinstance(found, bytes)
    return found
