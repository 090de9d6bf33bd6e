"""Simulated learners who practise by our rule, at random and in blocks; nothing here is part of the app."""
