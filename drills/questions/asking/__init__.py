"""The ways of asking, one frozen class each."""
