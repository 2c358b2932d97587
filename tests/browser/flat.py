"""A browser without drawing in space, for tests of what is flat."""

from __future__ import annotations

FLAT = """{
  const whole = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
    return kind === "webgl2" ? null : whole.call(this, kind, ...rest);
  };
}"""
