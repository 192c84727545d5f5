"""Lossless reading and writing of what is kept in files. Nothing here rounds.

What a person writes is read into the trade's values with every fault told at once, by its place and
line; what a program asks for is written so that exact values stay exact.
"""
