"""The curve of a form's pass rule, drawn."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING

from tinwright.examining.claims import claims_of_key, curve_of
from tinwright.figures import CurveMark, CurvePoint, pass_curve_svg
from tinwright.printing import inked

if TYPE_CHECKING:
    from tinwright.examining.form import ExamKey

__all__ = ["drawn_curve", "printed_curve"]


def drawn_curve(key: ExamKey, *, id_prefix: str) -> str:
    """Draw how likely somebody passes a form by how much they know, as SVG."""
    claims = claims_of_key(key)
    points = [CurvePoint(share, chances.at_once, chances.same_day, in_all) for share, chances, in_all in curve_of(key)]
    marks = [
        CurveMark(claims.not_ready.share, "not ready"),
        CurveMark(claims.just_qualified.share, "just qualified"),
        CurveMark(claims.ready.share, "ready"),
    ]
    return pass_curve_svg(points, marks, title=f"Who passes form {key.form}", id_prefix=id_prefix)


def printed_curve(key: ExamKey) -> str:
    """Return the address of an image with the curve, in grays, for paper."""
    drawn = base64.b64encode(inked(drawn_curve(key, id_prefix="curve"), "p").encode())
    return f"data:image/svg+xml;base64,{drawn.decode('ascii')}"
