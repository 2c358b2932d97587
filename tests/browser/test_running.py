"""The fixtures of this folder: a bench that answers, a browser that draws."""

from __future__ import annotations


def test_the_browser_reaches_the_bench_and_draws_in_space(open_page, server):
    page = open_page(in_space=True)
    answer = page.request.get("/s/no-version/nothing.css")
    assert answer.status == 404
    page.goto("about:blank")
    drawn = page.evaluate("() => !!document.createElement('canvas').getContext('webgl2')")
    assert drawn, "the turning view's tests need WebGL2"
    assert not (server.data / "designs").exists()
