"""Intake: whatever is pasted, read into snapshots (see :mod:`triage.intake.read`)."""
