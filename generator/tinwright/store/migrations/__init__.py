"""Migrations of the store: each revision takes the tables one step on, and keeps what is in them."""
