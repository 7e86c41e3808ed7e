"""The recognisers, behind one small interface: sound in, what was heard out.

The interface is :mod:`assistant.ears.hearing`. Nothing here is loaded before it is
used, so that the program also works without the voice parts.
"""
