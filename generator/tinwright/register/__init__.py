"""The register of volunteers: people, what they sat and showed, and their certificates.

with open_register("register.db") as register:
    volunteer = register.add_volunteer("Ann Example", kitchen="Mill Street", added_on=date(2026, 5, 2))
    print(register.missing_for_certificate(volunteer.id, date(2026, 5, 2)))
"""

from tinwright.register.entries import (
    Certificate,
    Coaching,
    Erasure,
    ItemResponse,
    Practical,
    Sitting,
    Volunteer,
)
from tinwright.register.practicals import STEPS
from tinwright.register.register import Register, open_register

__all__ = [
    "STEPS",
    "Certificate",
    "Coaching",
    "Erasure",
    "ItemResponse",
    "Practical",
    "Register",
    "Sitting",
    "Volunteer",
    "open_register",
]
