"""A certificate as a signed file: keys, proofs, the list of revoked ones, checking, paper.

key = open_key(Path("signing-key.json"), passphrase)
print(issue(facts, key).document["id"])
"""
