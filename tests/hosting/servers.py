"""Real web servers with exactly the settings we print, under a path of two folders."""

from __future__ import annotations

import grp
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.site.hosting import Place, settings_text

if TYPE_CHECKING:
    from collections.abc import Iterator

PATH = "/a/b/"
_AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0
_MODULES = ("/usr/lib/apache2/modules", "/usr/lib64/httpd/modules", "/usr/libexec/apache2", "/usr/lib/httpd/modules")

_NGINX = """\
pid {work}/nginx.pid;
error_log {work}/error.log;
worker_processes 1;
{user}
events {{ worker_connections 64; }}
http {{
    access_log off;
    client_body_temp_path {work}/body;
    proxy_temp_path {work}/proxy;
    fastcgi_temp_path {work}/fastcgi;
    uwsgi_temp_path {work}/uwsgi;
    scgi_temp_path {work}/scgi;
    server {{
        listen 127.0.0.1:{port};
{settings}
    }}
}}
"""

_APACHE = """\
ServerRoot "{work}"
ServerName https://127.0.0.1
Listen 127.0.0.1:{port}
PidFile "{work}/httpd.pid"
ErrorLog "{work}/error.log"
DefaultRuntimeDir "{work}"
{modules}
TypesConfig /dev/null
{user}
Alias "{path}" "{site}"
<Directory "{site}">
    Require all granted
    AllowOverride FileInfo Indexes
</Directory>
"""


def nobody() -> tuple[str, str]:
    """Name and group of the user without rights; a server must not serve as root."""
    user = pwd.getpwnam("nobody")
    return user.pw_name, grp.getgrgid(user.pw_gid).gr_name


def the_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


@contextmanager
def run(command: list[str], address: str, log: Path) -> Iterator[str]:
    """Run a server in the foreground until the end of the block; yields the address of the site."""
    with log.open("a", encoding="utf-8") as said:
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=said)
    try:
        port = int(address.split(":")[2].split("/", maxsplit=1)[0])
        end = time.monotonic() + 120
        while time.monotonic() < end and process.poll() is None:
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.05)
        else:
            logs = "".join(file.read_text(encoding="utf-8") for file in log.parent.glob("*.log"))
            pytest.fail(f"{command[0]} does not start: {logs}")
        yield address
    finally:
        process.terminate()
        process.wait(timeout=120)


@contextmanager
def nginx(work: Path, framed_by: tuple[str, ...] = ()) -> Iterator[str]:
    """Run nginx with the settings we print for it."""
    program = shutil.which("nginx") or shutil.which("nginx", path="/usr/sbin:/usr/local/sbin")
    if program is None:
        pytest.fail("no nginx: install it", pytrace=False)
    place, port = Path(tempfile.mkdtemp(dir=work)), the_port()
    place.chmod(0o755)
    settings = settings_text("nginx", Place(path=PATH, folder=f"{work}/site/", framed_by=framed_by))
    file = place / "nginx.conf"
    user = "user {} {};".format(*nobody()) if _AS_ROOT else ""
    file.write_text(_NGINX.format(work=place, port=port, settings=settings, user=user), encoding="utf-8")
    command = [program, "-p", str(place), "-c", str(file), "-g", "daemon off;"]
    with run(command, f"http://127.0.0.1:{port}{PATH}", place / "said.log") as address:
        yield address


@contextmanager
def apache(work: Path, framed_by: tuple[str, ...] = ()) -> Iterator[str]:
    """Run Apache httpd with the settings we print for it, in an .htaccess file beside index.html."""
    program = shutil.which("apache2") or shutil.which("httpd") or shutil.which("apache2", path="/usr/sbin")
    folder = next((folder for folder in _MODULES if Path(folder).is_dir()), None)
    if program is None or folder is None:
        pytest.fail("no Apache httpd: install it", pytrace=False)
    place, port = Path(tempfile.mkdtemp(dir=work)), the_port()
    names = ["mpm_event", "unixd", "authz_core", "alias", "dir", "mime", "headers", "filter", "deflate"]
    modules = "\n".join(
        f'LoadModule {name}_module "{folder}/mod_{name}.so"'
        for name in names
        if Path(f"{folder}/mod_{name}.so").is_file()
    )
    file = place / "httpd.conf"
    user = "User {}\nGroup {}".format(*nobody()) if _AS_ROOT else ""
    values = {
        "work": place,
        "port": port,
        "modules": modules,
        "user": user,
        "path": PATH.rstrip("/"),
        "site": work / "site",
    }
    file.write_text(_APACHE.format(**values), encoding="utf-8")
    settings = settings_text("apache", Place(path=PATH, framed_by=framed_by))
    (work / "site" / ".htaccess").write_text(settings, encoding="utf-8")
    command = [program, "-f", str(file), "-D", "FOREGROUND"]
    with run(command, f"http://127.0.0.1:{port}{PATH}", place / "said.log") as address:
        yield address
