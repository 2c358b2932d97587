/**
 * The WebGL2 side of the turning view: triangles and sheets in, one picture out, only when asked.
 *
 * A fine picture has smooth edges and is drawn at twice the size (several samples a pixel leave holes between triangles
 * where no card helps); a rough one costs a third and is for the moment while the piece turns on such a machine.
 *
 * `painterFor` always returns an object. Where there is no WebGL2 it is one that does nothing and has `ready` false.
 */

import { FLOOR_FRAGMENT, FLOOR_VERTEX, PIECE_FRAGMENT, PIECE_VERTEX } from "./shaders.js";
import { STRIDE } from "./mesh.js";

/**
 * @typedef {"proof" | "live"} Slot
 * @typedef {{camera: import("../camera.js").Camera, slot: Slot | null, coating: number[], seam: number[],
 *   band: [number, number, number, number], join: [number, number], floor: {y: number, radius: number, dark: number} }}
 *   Scene colours in linear light
 */

const PARTS = [3, 3, 2, 2, 2];
/** A fine picture is drawn so many times larger each way: the mean of four pixels makes one. */
const FINER = 2;

/** What stands in where nothing can be drawn. */
class Nothing {
  ready = false;
  lost = false;
  size() {}
  shape() {}
  sheet() {}
  has() {
    return false;
  }
  draw() {}
  /** @returns {{done: () => boolean}} */
  fence() {
    return { done: () => true };
  }
  dispose() {}
}

/**
 * @param {HTMLCanvasElement} canvas
 * @param {{lost: () => void, back: () => void}} heard called when the graphics card's state goes and comes again
 * @returns {Painter | Nothing}
 */
export function painterFor(canvas, heard) {
  try {
    const gl = canvas.getContext?.("webgl2", { alpha: true, antialias: false, depth: true, powerPreference: "low-power" });
    return gl ? new Painter(canvas, gl, heard) : new Nothing();
  } catch {
    return new Nothing();
  }
}

class Painter {
  /**
   * @param {HTMLCanvasElement} canvas
   * @param {WebGL2RenderingContext} gl
   * @param {{lost: () => void, back: () => void}} heard
   */
  constructor(canvas, gl, heard) {
    this.canvas = canvas;
    this.gl = gl;
    this.ready = true;
    this.lost = false;
    this.pictures = 0;
    this.onLost = (event) => {
      event.preventDefault();
      this.lost = true;
      heard.lost();
    };
    this.onBack = () => {
      this.lost = false;
      this.begin();
      heard.back();
    };
    canvas.addEventListener("webglcontextlost", this.onLost);
    canvas.addEventListener("webglcontextrestored", this.onBack);
    this.begin();
  }

  begin() {
    const { gl } = this;
    this.piece = program(gl, PIECE_VERTEX, PIECE_FRAGMENT);
    this.floor = program(gl, FLOOR_VERTEX, FLOOR_FRAGMENT);
    /** @type {Record<string, {texture: WebGLTexture, width: number, height: number}>} */
    this.sheets = {};
    this.count = 0;
    this.vertices = gl.createBuffer();
    this.indices = gl.createBuffer();
    this.layout = gl.createVertexArray();
    gl.bindVertexArray(this.layout);
    gl.bindBuffer(gl.ARRAY_BUFFER, this.vertices);
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, this.indices);
    let offset = 0;
    PARTS.forEach((size, i) => {
      gl.enableVertexAttribArray(i);
      gl.vertexAttribPointer(i, size, gl.FLOAT, false, 4 * STRIDE, 4 * offset);
      offset += size;
    });
    this.floorLayout = gl.createVertexArray();
    this.corners = gl.createBuffer();
    gl.bindVertexArray(this.floorLayout);
    gl.bindBuffer(gl.ARRAY_BUFFER, this.corners);
    gl.bufferData(gl.ARRAY_BUFFER, new Float32Array([-1, -1, 1, -1, -1, 1, 1, 1]), gl.STATIC_DRAW);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 2, gl.FLOAT, false, 0, 0);
    gl.bindVertexArray(null);
    this.smooth = null;
  }

  /** @returns {{frame: WebGLFramebuffer, width: number, height: number}} room for a picture of twice the size */
  larger() {
    const { gl } = this;
    const width = FINER * this.canvas.width;
    const height = FINER * this.canvas.height;
    if (this.smooth?.width !== width || this.smooth?.height !== height) {
      this.forgetSmooth();
      const [colour, depth] = [gl.createRenderbuffer(), gl.createRenderbuffer()];
      const frame = gl.createFramebuffer();
      gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
      for (const [buffer, format, place] of [
        [colour, gl.RGBA8, gl.COLOR_ATTACHMENT0], [depth, gl.DEPTH_COMPONENT24, gl.DEPTH_ATTACHMENT],
      ]) {
        gl.bindRenderbuffer(gl.RENDERBUFFER, buffer);
        gl.renderbufferStorage(gl.RENDERBUFFER, format, width, height);
        gl.framebufferRenderbuffer(gl.FRAMEBUFFER, place, gl.RENDERBUFFER, buffer);
      }
      this.smooth = { frame, colour, depth, width, height };
    }
    return this.smooth;
  }

  forgetSmooth() {
    if (this.smooth) {
      this.gl.deleteFramebuffer(this.smooth.frame);
      this.gl.deleteRenderbuffer(this.smooth.colour);
      this.gl.deleteRenderbuffer(this.smooth.depth);
      this.smooth = null;
    }
  }

  /** @param {number} width @param {number} height device pixels */
  size(width, height) {
    if (this.canvas.width !== width || this.canvas.height !== height) {
      this.canvas.width = width;
      this.canvas.height = height;
    }
  }

  /** @param {import("./mesh.js").Mesh} mesh */
  shape({ vertices, indices }) {
    const { gl } = this;
    if (this.lost) {
      return;
    }
    gl.bindVertexArray(this.layout);
    gl.bindBuffer(gl.ARRAY_BUFFER, this.vertices);
    gl.bufferData(gl.ARRAY_BUFFER, vertices, gl.STATIC_DRAW);
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, indices, gl.STATIC_DRAW);
    gl.bindVertexArray(null);
    this.count = indices.length;
  }

  /**
   * @param {Slot} slot
   * @param {TexImageSource & {width: number, height: number}} source
   * @param {boolean} still whether it stays for a while, and is worth smaller copies of itself
   */
  sheet(slot, source, still) {
    const { gl } = this;
    if (this.lost) {
      return;
    }
    const { width, height } = source;
    let held = this.sheets[slot];
    if (held && (held.width !== width || held.height !== height)) {
      gl.deleteTexture(held.texture);
      held = undefined;
    }
    if (!held) {
      held = { texture: gl.createTexture(), width, height };
      this.sheets[slot] = held;
      gl.bindTexture(gl.TEXTURE_2D, held.texture);
      const levels = still ? 1 + Math.floor(Math.log2(Math.max(width, height))) : 1;
      gl.texStorage2D(gl.TEXTURE_2D, levels, gl.RGBA8, width, height);
      gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
      gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
      gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, still ? gl.LINEAR_MIPMAP_LINEAR : gl.LINEAR);
    }
    gl.bindTexture(gl.TEXTURE_2D, held.texture);
    gl.texSubImage2D(gl.TEXTURE_2D, 0, 0, 0, gl.RGBA, gl.UNSIGNED_BYTE, source);
    if (still) {
      gl.generateMipmap(gl.TEXTURE_2D);
    }
  }

  /** @param {Slot} slot @returns {boolean} */
  has(slot) {
    return slot in this.sheets;
  }

  /** @param {Scene} scene @param {boolean} fine */
  draw(scene, fine) {
    const { gl } = this;
    if (this.lost || !this.count) {
      return;
    }
    this.pictures += 1;
    const view = scene.camera.matrix();
    const room = fine ? this.larger() : { frame: null, width: this.canvas.width, height: this.canvas.height };
    gl.bindFramebuffer(gl.FRAMEBUFFER, room.frame);
    gl.viewport(0, 0, room.width, room.height);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    if (scene.camera.tilt > 0.5) {
      this.drawFloor(view, scene.floor);
    }
    this.drawPiece(view, scene, fine ? FINER : 1);
    if (fine) {
      const { width, height } = this.canvas;
      gl.bindFramebuffer(gl.READ_FRAMEBUFFER, room.frame);
      gl.bindFramebuffer(gl.DRAW_FRAMEBUFFER, null);
      gl.blitFramebuffer(0, 0, room.width, room.height, 0, 0, width, height, gl.COLOR_BUFFER_BIT, gl.LINEAR);
      gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    }
  }

  drawFloor(view, { y, radius, dark }) {
    const { gl, floor } = this;
    gl.useProgram(floor.program);
    gl.uniformMatrix4fv(floor.at("view"), false, view);
    gl.uniform2f(floor.at("floorAt"), y, 1.8 * radius);
    gl.uniform2f(floor.at("rest"), radius, dark);
    gl.bindVertexArray(this.floorLayout);
    gl.disable(gl.DEPTH_TEST);
    gl.disable(gl.CULL_FACE);
    gl.enable(gl.BLEND);
    gl.blendFuncSeparate(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA, gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
    gl.drawArrays(gl.TRIANGLE_STRIP, 0, 4);
  }

  drawPiece(view, { camera, slot, coating, seam, band, join }, grain) {
    const { gl, piece } = this;
    const { right, up, back, eye } = camera;
    gl.useProgram(piece.program);
    gl.uniformMatrix4fv(piece.at("view"), false, view);
    gl.uniformMatrix3fv(piece.at("toEye"), false, [
      right.x, up.x, back.x, right.y, up.y, back.y, right.z, up.z, back.z,
    ]);
    gl.uniform3f(piece.at("eye"), eye.x, eye.y, eye.z);
    gl.uniform3fv(piece.at("coating"), coating);
    gl.uniform3fv(piece.at("seamColour"), seam);
    gl.uniform4fv(piece.at("band"), band);
    gl.uniform3f(piece.at("join"), join[0], join[1], grain);
    const held = slot ? this.sheets[slot] : undefined;
    gl.uniform1f(piece.at("printed"), held ? 1 : 0);
    gl.activeTexture(gl.TEXTURE0);
    gl.bindTexture(gl.TEXTURE_2D, held ? held.texture : null);
    gl.uniform1i(piece.at("sheet"), 0);
    gl.bindVertexArray(this.layout);
    gl.disable(gl.BLEND);
    gl.enable(gl.DEPTH_TEST);
    gl.enable(gl.CULL_FACE);
    gl.drawElements(gl.TRIANGLES, this.count, gl.UNSIGNED_INT, 0);
    gl.bindVertexArray(null);
  }

  /** @returns {{done: () => boolean}} done once the card has carried out all that was asked until now */
  fence() {
    const { gl } = this;
    const sync = this.lost ? null : gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    if (!sync) {
      return { done: () => true };
    }
    gl.flush();
    let over = false;
    return {
      done: () => {
        if (!over && (this.lost || gl.getSyncParameter(sync, gl.SYNC_STATUS) !== gl.UNSIGNALED)) {
          over = true;
          gl.deleteSync(sync);
        }
        return over;
      },
    };
  }

  /** Free everything, the context too. */
  dispose() {
    const { gl, canvas } = this;
    canvas.removeEventListener("webglcontextlost", this.onLost);
    canvas.removeEventListener("webglcontextrestored", this.onBack);
    for (const { texture } of Object.values(this.sheets)) {
      gl.deleteTexture(texture);
    }
    this.forgetSmooth();
    gl.deleteBuffer(this.vertices);
    gl.deleteBuffer(this.indices);
    gl.deleteBuffer(this.corners);
    gl.deleteVertexArray(this.layout);
    gl.deleteVertexArray(this.floorLayout);
    gl.deleteProgram(this.piece.program);
    gl.deleteProgram(this.floor.program);
    gl.getExtension("WEBGL_lose_context")?.loseContext();
    this.sheets = {};
    this.count = 0;
    this.ready = false;
    this.lost = true;
  }
}

/** @returns {{program: WebGLProgram, at: (name: string) => WebGLUniformLocation | null}} */
function program(gl, vertex, fragment) {
  const made = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(made, shader);
    gl.deleteShader(shader);
  }
  gl.linkProgram(made);
  if (!gl.getProgramParameter(made, gl.LINK_STATUS) && !gl.isContextLost()) {
    throw new Error(gl.getProgramInfoLog(made) ?? "The shader did not link.");
  }
  const places = new Map();
  return {
    program: made,
    at(name) {
      if (!places.has(name)) {
        places.set(name, gl.getUniformLocation(made, name));
      }
      return places.get(name);
    },
  };
}
