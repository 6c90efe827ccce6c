"""Programs that try to break the binder, and count: `sh script/proof` runs them all.

They may import anything of `binder`; nothing of `binder` imports them. Whatever they do hangs
on a seed, so that what broke once can be broken again.
"""
