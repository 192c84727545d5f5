"""The only room that rounds: exact values turned into what a person reads.

Rounding is half away from zero, once, at the last step. The words of methods, settings, readings
and cautions live here, so that page, sheet and command say the same.
"""
