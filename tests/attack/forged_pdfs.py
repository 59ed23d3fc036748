"""PDF files made to be read in two ways, to cost much, or to break who reads them; each with the answer both must give."""

from __future__ import annotations

import io
import zlib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import pikepdf

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Pdf", "forged_pdfs", "repacked"]

SPEC = b"<< /Type /Filespec /F (certificate.json) /UF (certificate.json) /AFRelationship /Data /EF << /F 5 0 R /UF 5 0 R >> >>"
CATALOG = b"<< /Type /Catalog /Pages 2 0 R /Names << /EmbeddedFiles 3 0 R >> /AF [ 4 0 R ] >>"


def stream(content: bytes, entries: bytes = b"") -> bytes:
    return b"<< /Length %d %b >>\nstream\n%b\nendstream" % (len(content), entries, content)


@dataclass
class Pdf:
    """A small PDF with one attached file, of which any part can be said otherwise."""

    attached: bytes
    objects: dict[int, bytes] = field(default_factory=dict)
    trailer: bytes = b""
    before: bytes = b""
    """Written after the head, where nothing leads to."""

    def text(self) -> bytes:
        parts = {
            1: CATALOG,
            2: b"<< /Type /Pages /Kids [ 10 0 R ] /Count 1 >>",
            10: b"<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 612 792 ] >>",
            3: b"<< /Names [ (certificate.json) 4 0 R ] >>",
            4: SPEC,
            5: stream(self.attached, b"/Type /EmbeddedFile"),
        } | self.objects
        out = bytearray(b"%PDF-1.7\n" + self.before)
        places = [(0, b"0000000000 65535 f \n")]
        for number, content in sorted(parts.items()):
            places.append((number, b"%010d 00000 n \n" % len(out)))
            out += b"%d 0 obj\n%b\nendobj\n" % (number, content)
        start = len(out)
        rows = b"".join(b"%d 1\n%b" % place for place in places)
        out += b"xref\n%btrailer\n<< /Root 1 0 R /Size %d %b >>\n" % (rows, max(parts) + 1, self.trailer)
        return bytes(out + b"startxref\n%d\n%%%%EOF\n" % start)


def updated(pdf: bytes, number: int, content: bytes) -> bytes:
    """Add a newer version of one object to the end of a file, as programs do that save changes only."""
    start = int(pdf.rsplit(b"startxref", 1)[1].split()[0])
    out = pdf + b"%d 0 obj\n%b\nendobj\n" % (number, content)
    row = b"%d 1\n%010d 00000 n \n" % (number, len(pdf))
    return out + b"xref\n%btrailer\n<< /Root 1 0 R /Prev %d >>\nstartxref\n%d\n%%%%EOF\n" % (row, start, len(out))


def repacked(pdf: bytes, **how: object) -> bytes:
    """Save a file by another program."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        opened.save(out, **how)
    return out.getvalue()


def forged_pdfs(genuine: bytes, other: bytes, altered: bytes) -> Iterator[tuple[str, bytes, str]]:
    """Yield name, content and answer: `genuine`, `other` (genuine, of the other person) or `refused`.

    Args:
        genuine: a certificate.
        other: somebody else's.
        altered: one that was tampered with.
    """
    plain = Pdf(genuine).text()
    modes = pikepdf.ObjectStreamMode
    yield "plain", plain, "genuine"
    yield "packed anew", repacked(plain, compress_streams=True, object_stream_mode=modes.generate), "genuine"
    yield "for the web", repacked(plain, linearize=True), "genuine"
    yield "for the web, packed", repacked(plain, linearize=True, object_stream_mode=modes.generate), "genuine"
    yield "letters after the end", plain + b"\n" * 500, "genuine"
    yield (
        "length elsewhere",
        Pdf(genuine, {5: stream(genuine).replace(b"%d" % len(genuine), b"6 0 R", 1), 6: b"%d" % len(genuine)}).text(),
        "genuine",
    )
    yield (
        "name in wide letters",
        Pdf(
            genuine,
            {
                4: SPEC.replace(
                    b"(certificate.json)", b"<FEFF" + "certificate.json".encode("utf-16-be").hex().encode() + b">"
                )
            },
        ).text(),
        "genuine",
    )
    yield "name with an escape", Pdf(genuine, {4: SPEC.replace(b"(cert", rb"(\143ert")}).text(), "genuine"
    yield (
        "tree of names",
        Pdf(genuine, {3: b"<< /Kids [ 6 0 R ] >>", 6: b"<< /Names [ (a) 4 0 R ] >>"}).text(),
        "genuine",
    )
    yield "saved with another certificate", updated(plain, 5, stream(other)), "other"
    yield "saved with an altered one", updated(plain, 5, stream(altered)), "refused"
    yield from _attachments(genuine, other, altered)
    yield from _locked(plain)
    yield from _costly(genuine)
    yield from _broken(genuine, plain)


def _attachments(genuine: bytes, other: bytes, altered: bytes) -> Iterator[tuple[str, bytes, str]]:
    loose = b"9 0 obj\n" + stream(genuine, b"/Type /EmbeddedFile") + b"\nendobj\n"
    second = {6: SPEC.replace(b"5 0 R", b"7 0 R"), 7: stream(other, b"/Type /EmbeddedFile")}
    yield "altered, a genuine one loose before", Pdf(altered, before=loose).text(), "refused"
    yield "none, a genuine one loose", Pdf(genuine, {3: b"<< /Names [] >>"}, before=loose).text(), "refused"
    yield "one loose before, another linked", Pdf(other, before=loose).text(), "other"
    for name, names in {"two, ours first": b"(a) 4 0 R (b) 6 0 R", "two, ours last": b"(a) 6 0 R (b) 4 0 R"}.items():
        yield name, Pdf(genuine, {3: b"<< /Names [ " + names + b" ] >>", **second}).text(), "refused"
    yield (
        "two in two branches",
        Pdf(
            genuine, {3: b"<< /Names [ (a) 4 0 R ] /Kids [ 8 0 R ] >>", 8: b"<< /Names [ (b) 6 0 R ] >>", **second}
        ).text(),
        "refused",
    )
    yield "the same twice", Pdf(genuine, {3: b"<< /Names [ (a) 4 0 R (b) 4 0 R ] >>"}).text(), "refused"
    for name, old, new in (
        ("other name", b"certificate.json", b"notes.json"),
        ("two names", b"/UF (certificate.json)", b"/UF (other.json)"),
        ("no name", b"/F (certificate.json) /UF (certificate.json)", b""),
        ("name as a name", b"(certificate.json)", b"/certificate.json"),
        ("other relation", b"/Data", b"/Supplement"),
        ("no relation", b"/AFRelationship /Data", b""),
        ("relation in a list", b"/Data", b"[ /Data ]"),
        ("relation in a dictionary", b"/Data", b"<< /Data /Data >>"),
        ("two files in one", b"/UF 5 0 R", b"/UF 7 0 R"),
        ("an entry twice", b"/EF", b"/EF << /F 7 0 R >> /EF"),
        ("no file", b"/EF << /F 5 0 R /UF 5 0 R >>", b""),
        ("file outside", b"5 0 R", b"(certificate.json)"),
    ):
        yield name, Pdf(genuine, {4: SPEC.replace(old, new), **second}).text(), "refused"
    for name, old, new in (
        ("belongs to nothing", b"/AF [ 4 0 R ]", b""),
        ("another belongs", b"/AF [ 4 0 R ]", b"/AF [ 6 0 R ]"),
        ("two belong", b"/AF [ 4 0 R ]", b"/AF [ 4 0 R 6 0 R ]"),
        ("no tree", b"/Names << /EmbeddedFiles 3 0 R >>", b""),
        ("tree a number", b"3 0 R >>", b"3 >>"),
    ):
        yield name, Pdf(genuine, {1: CATALOG.replace(old, new), **second}).text(), "refused"


def _locked(plain: bytes) -> Iterator[tuple[str, bytes, str]]:
    for strength in (3, 4, 6):
        for words in ("open sesame", ""):
            lock = pikepdf.Encryption(owner="owner", user=words, R=strength, aes=strength > 3, metadata=strength > 3)
            yield f"locked, strength {strength}, {words or 'no'} password", repacked(plain, encryption=lock), "refused"


def _costly(genuine: bytes) -> Iterator[tuple[str, bytes, str]]:
    empty = zlib.compress(bytes(30_000_000), 9)
    twice = zlib.compress(zlib.compress(bytes(300_000_000), 9), 9)
    for name, packed, filters in (
        ("bomb", empty, b"/Filter /FlateDecode"),
        ("bomb in a bomb", twice, b"/Filter [ /FlateDecode /FlateDecode ]"),
        ("letters after what is packed", zlib.compress(genuine) + b"x", b"/Filter /FlateDecode"),
        ("packed and cut short", zlib.compress(genuine)[:-2], b"/Filter /FlateDecode"),
        ("packed another way", genuine, b"/Filter /LZWDecode"),
        ("predicted without end", zlib.compress(genuine), b"/Filter /FlateDecode /DecodeParms << /Predictor 12 /Columns 2147483647 >>"),
        ("predicted by a paragon", zlib.compress(genuine), b"/Filter /FlateDecode /DecodeParms << /Predictor true >>"),
    ):  # fmt: skip
        yield name, Pdf(genuine, {5: stream(packed, filters)}).text(), "refused"
    pack = b"/Type /ObjStm /N 999999999 /First 0 /Filter /FlateDecode"
    rows = b"\x01\x00\x00\x0f\x00\x02\x00\x07\x00" * 3
    table = b"7 0 obj\n" + stream(rows, b"/Type /XRef /W [ 1 3 1 ] /Index [ 0 999999999 ] /Root 1 0 R") + b"\nendobj\n"
    yield "table without end", b"%PDF-1.7\n" + table + b"startxref\n9\n%%EOF", "refused"
    yield "pack without end", _by_pack(stream(empty, pack)), "refused"
    yield (
        "pack in itself",
        _by_pack(stream(b"7 0 ", b"/Type /ObjStm /N 1 /First 4").replace(b"/Length 4", b"/Length 1 0 R")),
        "refused",
    )
    for letter in (b"[", b"<<", b"<< /A ", b"(", b"<", b"%", b"\\(", b"/", b"1 ", b"1 0 ", b"[1 0 R]"):
        yield f"catalog of {letter.decode()}", Pdf(genuine, {1: letter * (500_000 // len(letter))}).text(), "refused"
    yield (
        "a hundred thousand kids",
        Pdf(
            genuine, {3: b"<< /Kids [" + b" 6 0 R" * 2_000 + b"] >>", 6: b"<< /Names [" + b"1 " * 7_000 + b"] >>"}
        ).text(),
        "refused",
    )
    yield "kids of themselves", Pdf(genuine, {3: b"<< /Kids [ 3 0 R 3 0 R ] >>"}).text(), "refused"
    yield "blanks", b"%PDF-1.7\n" + b" " * 4_900_000 + b"startxref\n9\n%%EOF", "refused"
    yield "starts", b"%PDF-1.7\n" + b"startxref " * 490_000, "refused"


def _by_pack(pack: bytes) -> bytes:
    """Return a file whose catalog lies in a pack."""
    out = bytearray(b"%PDF-1.7\n")
    places = b""
    for number, content in ((7, pack),):
        places += b"\x01" + len(out).to_bytes(3) + b"\x00"
        out += b"%d 0 obj\n%b\nendobj\n" % (number, content)
    start = len(out)
    rows = b"\x02\x00\x00\x07\x00" + places
    out += b"8 0 obj\n%b\nendobj\n" % stream(rows, b"/Type /XRef /W [ 1 3 1 ] /Index [ 1 1 7 1 ] /Root 1 0 R")
    return bytes(out) + b"startxref\n%d\n%%%%EOF\n" % start


def _broken(genuine: bytes, plain: bytes) -> Iterator[tuple[str, bytes, str]]:
    start = plain.rsplit(b"startxref\n", 1)[1].split()[0]
    for name, place in (
        ("nowhere", b"0"),
        ("beyond", b"99999999"),
        ("negative", b"-1"),
        ("far", b"9" * 400),
        ("text", b"x"),
    ):
        yield f"begins {name}", plain.replace(b"startxref\n" + start, b"startxref\n" + place), "refused"
    yield "cut in half", plain[: len(plain) // 2], "refused"
    yield "without its end", plain[: plain.rindex(b"startxref")], "refused"
    yield "head alone", b"%PDF-1.7", "refused"
    for name, trailer in (
        ("table after itself", b"/Prev " + start),
        ("table before a text", b"/Prev (x)"),
        ("table before a fraction", b"/Prev 9.0"),
        ("table before no table", b"/Prev 9"),
    ):
        yield name, Pdf(genuine, trailer=trailer).text(), "refused"
    yield "root in nothing", plain.replace(b"/Root 1 0 R", b"/Root 9 0 R"), "refused"
    yield "root a stream's length", plain.replace(b"/Root 1 0 R", b"/Root 5 0 R"), "refused"
    yield "object of another number", plain.replace(b"\n4 0 obj", b"\n6 0 obj"), "refused"
    yield "object of another generation", plain.replace(b"\n4 0 obj", b"\n4 1 obj"), "refused"
    for length in (b"/Length 1", b"/Length -5", b"/Length 5 0 R", b"/Length 9999999999", b"/Length true", b""):
        changed = stream(genuine).replace(b"/Length %d" % len(genuine), length)
        yield f"stream of {length.decode()!r}", Pdf(genuine, {5: changed}).text(), "refused"
    yield "attached a number", Pdf(genuine, {5: b"5"}).text(), "refused"
