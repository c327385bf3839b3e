"""Many wearers of one sheet: a draft for each row of a table, and what to buy for all.

    from pathlib import Path
    import render

    done = render.write_batch(Path("chorus.csv"), Path("chorus-skirt.toml"), Path("chorus"))
    print(done.drafted, done.faulty)

``writing`` leads: ``rows`` hands on one task a row, ``running`` runs them on this machine or on
a cluster, ``task`` drafts one, ``journal`` keeps what came back, ``summary`` tells of it.
"""
