"""The tables of the store, as its newest migration leaves them."""

from __future__ import annotations

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    Date,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    false,
)

__all__ = [
    "ALL_TABLES",
    "bench_choice",
    "bench_event",
    "bench_header",
    "bench_import",
    "bench_session",
    "certificate",
    "change",
    "coaching",
    "counter",
    "erasure",
    "item_response",
    "metadata",
    "practical",
    "sitting",
    "voided",
    "volunteer",
]

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)
"""Every constraint has a name, so that a later migration can change it on either database."""

counter = Table(
    "counter",
    metadata,
    Column("name", Text, primary_key=True),
    Column("last", Integer, nullable=False),
)
"""Last number given out for each kind of id; numbers are never given twice."""

change = Table(
    "change",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("subject", Text, nullable=False),
)
"""Who did what to which id, and when. Triggers refuse to change or delete a line."""

erasure = Table(
    "erasure",
    metadata,
    Column("volunteer_id", Text, primary_key=True),
    Column("erased_on", Date, nullable=False),
)

volunteer = Table(
    "volunteer",
    metadata,
    Column("id", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("email", Text),
    Column("kitchen", Text),
    Column("added_on", Date, nullable=False),
)

sitting = Table(
    "sitting",
    metadata,
    Column("id", Text, primary_key=True),
    Column("volunteer_id", Text, ForeignKey("volunteer.id")),
    Column("exam", Text, nullable=False),
    Column("form", Text, nullable=False),
    Column("taken_on", Date, nullable=False),
    Column("score", Text, nullable=False),
    Column("out_of", Text, nullable=False),
    Column("passed", Boolean, nullable=False),
    Column("digest", Text, nullable=False),
    Column("graded_with", Text, nullable=False),
    Column("profile", JSON, nullable=False),
    Column("supersedes", Text, ForeignKey("sitting.id")),
    Column("second_of", Text, ForeignKey("sitting.id")),
    Column("allowed", Text),
    Column("public_bank", Boolean, nullable=False, server_default=false()),
    UniqueConstraint("digest", "graded_with"),
    UniqueConstraint("supersedes"),
    Index(None, "volunteer_id"),
    Index(None, "exam", "form"),
)
"""A sitting without a volunteer is what an erasure left for the statistics."""

item_response = Table(
    "item_response",
    metadata,
    Column("sitting_id", Text, ForeignKey("sitting.id"), primary_key=True),
    Column("item_id", Text, primary_key=True),
    Column("response", Text),
    Column("score", Text, nullable=False),
    Index(None, "item_id"),
)

practical = Table(
    "practical",
    metadata,
    Column("id", Text, primary_key=True),
    Column("volunteer_id", Text, ForeignKey("volunteer.id"), nullable=False),
    Column("drive", Text, nullable=False),
    Column("sealer", Text),
    Column("observed_on", Date, nullable=False),
    Column("examiner", Text, nullable=False),
    Column("passed", Boolean, nullable=False),
    Column("steps", JSON, nullable=False),
    Index(None, "volunteer_id"),
)

coaching = Table(
    "coaching",
    metadata,
    Column("id", Text, primary_key=True),
    Column("volunteer_id", Text, ForeignKey("volunteer.id"), nullable=False),
    Column("coached_on", Date, nullable=False),
    Column("coach", Text, nullable=False),
    Column("about", Text, nullable=False),
    Index(None, "volunteer_id"),
)

voided = Table(
    "voided",
    metadata,
    Column("kind", Text, primary_key=True),
    Column("id", Text, primary_key=True),
    Column("voided_on", Date, nullable=False),
    Column("reason", Text, nullable=False),
)
"""Sittings and practical checks that do not count: entered by mistake. They stay, so that it can be seen."""

certificate = Table(
    "certificate",
    metadata,
    Column("id", Text, primary_key=True),
    Column("volunteer_id", Text, ForeignKey("volunteer.id")),
    Column("name", Text, nullable=False),
    Column("drives", JSON, nullable=False),
    Column("exam", Text, nullable=False),
    Column("form", Text, nullable=False),
    Column("issued_on", Date, nullable=False),
    Column("valid_until", Date, nullable=False),
    Column("revoked_on", Date),
    Column("revoked_reason", Text),
    Column("renews", Text, ForeignKey("certificate.id")),
    Column("sitting_id", Text, ForeignKey("sitting.id")),
    Column("practical_ids", JSON, nullable=False),
    Column("public_bank", Boolean, nullable=False, server_default=false()),
    Index(None, "volunteer_id"),
    Index(None, "revoked_on"),
)
"""`sitting_id` and `practical_ids` say what it rests on; an erasure empties them with the person."""

bench_import = Table(
    "bench_import",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("digest", Text, nullable=False),
    Column("file", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    UniqueConstraint("digest"),
)
"""Files of the bench log that were taken in, by the digest of their bytes."""

bench_session = Table(
    "bench_session",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("date", Text, nullable=False),
    Column("kitchen", Text, nullable=False),
    Column("sealer", Text, nullable=False),
    UniqueConstraint("date", "kitchen", "sealer"),
)

bench_header = Table(
    "bench_header",
    metadata,
    Column("session", Integer, ForeignKey("bench_session.number"), primary_key=True),
    Column("source", Text, primary_key=True),
    Column("digest", Text, primary_key=True),
    Column("weight", Integer, nullable=False),
    Column("can", Text, nullable=False),
    Column("lid_lot", Text, nullable=False),
    Column("supervisor", Text, nullable=False),
    Column("product", Text, nullable=False),
)
"""What each telephone or sheet says at the head of a session; `weight` grows with what it had written by then."""

bench_event = Table(
    "bench_event",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("session", Integer, ForeignKey("bench_session.number"), nullable=False),
    Column("id", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("digest", Text, nullable=False),
    Column("counts", Boolean, nullable=False),
    Column("import_number", Integer, ForeignKey("bench_import.number")),
    Column("at", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("struck", Boolean, nullable=False),
    Column("by", Text, nullable=False),
    Column("can_number", Integer),
    Column("first", Integer),
    Column("last", Integer),
    Column("result", Text, nullable=False),
    Column("can", Text, nullable=False),
    Column("lid_lot", Text, nullable=False),
    Column("defect", Text, nullable=False),
    Column("cause", Text, nullable=False),
    Column("adjuster", Text, nullable=False),
    Column("direction", Text, nullable=False),
    Column("turns", Text, nullable=False),
    Column("method", Text, nullable=False),
    Column("specification", Text, nullable=False),
    Column("readings", Text, nullable=False),
    Column("torn_down", Boolean, nullable=False),
    Column("reason", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("run", Text, nullable=False),
    Column("on", Text, nullable=False),
    Column("after", Text, nullable=False),
    UniqueConstraint("session", "id", "revision", "digest"),
)
"""Every version of every event, the `digest` being that of its content; of one event, one version `counts`.

The entries are those of `benchlog.Event`: blank texts are empty, readings are JSON."""

bench_choice = Table(
    "bench_choice",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("session", Integer, ForeignKey("bench_session.number"), nullable=False),
    Column("event_id", Text, nullable=False),
    Column("digest", Text, nullable=False),
    Column("among", JSON, nullable=False),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("reason", Text, nullable=False),
    Index(None, "session", "event_id"),
)
"""What somebody decided between versions that disagree; `event_id` is empty where it is about the head."""

ALL_TABLES = tuple(metadata.sorted_tables)
"""Every table, those that others refer to first."""
