"""The command that prints the settings, and the policy in them."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from tinwright.cli import main
from tinwright.site.hosting import SERVERS, Place, content_security_policy, settings_text


def rules(policy: str) -> dict[str, list[str]]:
    return {rule.split()[0]: rule.split()[1:] for rule in policy.split(";")}


def test_the_policy_allows_nothing_inline_and_nothing_from_elsewhere() -> None:
    found = rules(content_security_policy())
    assert found["default-src"] == ["'none'"]
    assert {word for words in found.values() for word in words} == {"'none'", "'self'", "data:"}
    assert [name for name, words in found.items() if "data:" in words] == ["img-src"]
    assert found["base-uri"] == found["form-action"] == ["'none'"]


def test_only_the_frames_are_the_web_teams_choice() -> None:
    plain, framed = rules(content_security_policy()), rules(content_security_policy(["https://extension.example.edu"]))
    assert framed.pop("frame-ancestors") == ["'self'", "https://extension.example.edu"]
    plain.pop("frame-ancestors")
    assert plain == framed


@pytest.mark.parametrize("server", SERVERS)
def test_the_command_prints_the_settings_for_a_place(server: str) -> None:
    arguments = ["hosting", server, "--path", "/food/sealing/", "--framed-by", "https://extension.example.edu"]
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == 0
    place = Place(path="/food/sealing/", framed_by=("https://extension.example.edu",))
    assert result.output == settings_text(server, place)
    assert "frame-ancestors 'self' https://extension.example.edu" in result.output
    assert "/food/sealing/404.html" in result.output


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--path", "food"], "expected a path from slash to slash such as /food/sealing/, got 'food'"),
        (["--path", '/a"; evil/'], "expected a path from slash to slash"),
        (["--path", "/a/\n/"], "expected a path from slash to slash"),
        (["--folder", "/srv/$(x)"], "expected a folder such as /srv/www/sealing/, got '/srv/$(x)'"),
        (["--framed-by", "*"], "expected a site such as https://extension.example.edu, got '*'"),
        (["--framed-by", "https://a.example; script-src *"], "expected a site such as https://extension.example.edu"),
    ],
)
def test_what_cannot_stand_in_the_settings_is_refused(arguments: list[str], said: str) -> None:
    result = CliRunner().invoke(main, ["hosting", "nginx", *arguments])
    assert result.exit_code == 2
    assert said in result.output
    assert "location" not in result.output
