"""A row of stickers found among edges: with noise, gaps, and edges that belong to none."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.edge_grid import Edge, EdgeGrid, find_grid

WITHIN = 1.2


@given(
    count=st.integers(1, 12),
    margin=st.floats(3, 20),
    size=st.floats(12, 60),
    gap=st.sampled_from([0.0, 2.0, 3.5, 9.0]),
    shake=st.lists(st.floats(-0.2, 0.2), min_size=24, max_size=24),
)
def test_an_even_row_is_found_again(
    count: int, margin: float, size: float, gap: float, shake: list[float]
) -> None:
    row = EdgeGrid(count, margin, size + gap, size)
    seen = row.edges_mm if gap else sorted({round(place, 6) for place in row.edges_mm})
    edges = [Edge(place + off, 10.0) for place, off in zip(seen, shake, strict=False)]
    found = find_grid(edges, WITHIN)
    assert found is not None
    assert found.count == count
    assert abs(found.size_mm - size) < 1.0
    assert abs(found.near_mm(count - 1) - row.near_mm(count - 1)) < 1.0


def test_strange_edges_and_missing_ones_do_not_put_it_off() -> None:
    row = EdgeGrid(5, 8.0, 40.0, 37.0)
    places = [place for at, place in enumerate(row.edges_mm) if at != 3]
    edges = [Edge(place, 10.0) for place in places] + [Edge(21.0, 2.0), Edge(3.0, 2.0)]
    found = find_grid(edges, WITHIN)
    assert found is not None
    assert (found.count, round(found.margin_mm), round(found.pitch_mm)) == (5, 8, 40)


def test_edges_without_order_are_no_row() -> None:
    places = [5.0, 11.3, 31.0, 37.9, 71.1, 93.0, 99.7, 140.0, 151.0]
    assert find_grid([Edge(place, 10.0) for place in places], 0.3) is None
    assert find_grid([], WITHIN) is None
