"""Checks: functions from the model to findings, one module to a family."""
