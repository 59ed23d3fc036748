"""The scripts of the site, by subject: plain scripts, no modules, no framework.

    from tinwright.browser import needed_scripts

    needed_scripts("quiz.js")

A folder is a subject; the site publishes the scripts of all subjects side by side, by their names. `examination` goes
into the page of an examination alone, and `worker` becomes the site's service worker. `globals.d.ts` says of what type
each thing is that one script hands to another. A script begins with what it needs, and where it goes:

    // needs: quiz-scoring.js quiz-store.js
    // joined: quiz.js
"""

from __future__ import annotations

from tinwright.browser.scripts import SUBJECTS, Script, needed_scripts, published_scripts, script_text, scripts

__all__ = ["SUBJECTS", "Script", "needed_scripts", "published_scripts", "script_text", "scripts"]
