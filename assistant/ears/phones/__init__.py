"""A second opinion: compares the phones of a sentence, one after the other, with the sound.

The first model writes whole sentences and prefers well-formed ones; it will finish a word that
was broken off. This one, a hidden Markov model of phones, knows no words. It says how well each
sentence that may be meant fits, phone by phone, and where it does not.
"""
