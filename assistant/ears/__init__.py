"""The recognisers, behind one small seam: sound in, what was heard out.

The seam is :mod:`assistant.ears.hearing`. Nothing here is loaded before it is
used, so that a program without the voice parts works as before.
"""
