"""Measuring a real head: readings, the wave fitted to them, how good it is, and whether it agrees.

A parked head shows plate -> pitch (lead, gain, evenness). It does not show the lag.
"""
