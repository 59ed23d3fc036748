"""A certificate as a signed file: the office's keys, proofs, the list of revoked ones, checking, and the printed page.

key = open_key(Path("signing-key.json"), passphrase)
print(issue(facts, key).document["id"])
"""
