"""Every table of the contributors' guide under "Measured": python -m tests.measure."""

from tests.measure import checking, drills, layers

for table in (drills, layers, checking):
    table.main()
    print()
