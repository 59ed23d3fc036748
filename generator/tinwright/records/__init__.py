"""The educator's private records, and the signed certificates made from them."""
