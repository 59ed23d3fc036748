"""Where private data lies: tables, whole transactions, migrations, the change record.

One file (SQLite), or a PostgreSQL database when several computers write to it. Nothing of it is ever published but the
ids of revoked certificates.

with open_store("register.db") as store, store.reading() as connection:
    print(connection.execute(select(tables.volunteer)).all())
"""

from tinwright.store.exporting import csv_tables
from tinwright.store.place import check_place, write_private
from tinwright.store.store import Store, open_store

__all__ = ["Store", "check_place", "csv_tables", "open_store", "write_private"]
