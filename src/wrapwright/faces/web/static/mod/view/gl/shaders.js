/**
 * The light: a window to the upper left, a softer one to the right, a bright ceiling, and a thin rim.
 *
 * The even part is that of the printed proof: the side that faces us comes out near 1, so that a colour there is the
 * colour it has. The print lies in the coating as dye does: light of the print times light of the coating.
 */

export const PIECE_VERTEX = `#version 300 es
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec2 sheetAt;
layout(location = 3) in vec2 bandAt;
layout(location = 4) in vec2 look;
uniform mat4 view;
out vec3 vPlace;
out vec3 vNormal;
out vec2 vSheet;
out vec2 vBand;
out vec2 vLook;
void main() {
  vPlace = place;
  vNormal = normal;
  vSheet = sheetAt;
  vBand = bandAt;
  vLook = look;
  gl_Position = view * vec4(place, 1.0);
}`;

export const PIECE_FRAGMENT = `#version 300 es
precision highp float;
in vec3 vPlace;
in vec3 vNormal;
in vec2 vSheet;
in vec2 vBand;
in vec2 vLook;
uniform mat3 toEye;       // space -> right, up, towards the eye
uniform vec3 eye;
uniform sampler2D sheet;
uniform float printed;    // 0: no sheet yet
uniform vec3 coating;     // linear light
uniform vec4 band;        // height, lower length of a turn, its growth a mm, half of the handle's gap
uniform vec3 join;        // overlap mm, 1 when a seam is shown, width of its line in pixels
uniform vec3 seamColour;  // linear light
out vec4 colour;

// A power law serves for both ways: what is not shaded comes out as it went in, code for code.
vec3 linear(vec3 c) { return pow(c, vec3(2.2)); }
vec3 encoded(vec3 c) { return pow(clamp(c, 0.0, 1.0), vec3(1.0 / 2.2)); }
float within(float way, float unit) { return clamp(way / unit + 0.5, 0.0, 1.0); }
float lamp(float side, float middle, float half_, float soft) {
  return 1.0 - smoothstep(half_, half_ + soft, abs(side - middle));
}

vec3 surface(float facing) {
  vec2 unit = clamp(fwidth(vBand), vec2(1e-4), vec2(1.5));
  float turn = band.y + band.z * vBand.y;
  float inBand = within(vBand.y, unit.y) * within(band.x - vBand.y, unit.y);
  float art = inBand;
  if (band.w > 0.0) {
    art *= within(vBand.x - band.w, unit.x) * within(turn - band.w - vBand.x, unit.x);
  }
  vec3 skin = coating;
  if (printed > 0.5 && art > 0.0) {
    skin *= mix(vec3(1.0), linear(texture(sheet, vSheet).rgb), art);
  }
  if (join.y > 0.5) {
    float wide = join.z * unit.x;
    float line = within(0.6 * wide - min(vBand.x, turn - vBand.x), unit.x) * inBand;
    float lap = within(0.5 * wide - abs(vBand.x - join.x), unit.x) * inBand * step(0.5, fract(vBand.y / 5.0));
    float shown = smoothstep(0.12, 0.35, facing);
    float glow = dot(seamColour, vec3(0.2126, 0.7152, 0.0722));
    // On a light ground the line must be dark whatever the page's own scheme is.
    vec3 ink = seamColour * (dot(skin, vec3(0.2126, 0.7152, 0.0722)) > 0.25 ? min(1.0, 0.12 / glow) : 1.0);
    skin = mix(skin, ink, shown * (0.85 * line + 0.40 * lap * step(0.01, join.x)));
  }
  return skin;
}

void main() {
  vec3 n = normalize(toEye * vNormal);
  vec3 v = normalize(toEye * (eye - vPlace));
  float facing = clamp(dot(n, v), 0.0, 1.0);
  float key = clamp((dot(n, vec3(-0.520, 0.460, 0.720)) + 0.25) / 1.25, 0.0, 1.0);
  float fill = clamp(dot(n, vec3(0.816, 0.153, 0.561)), 0.0, 1.0);
  float edge = 1.0 - facing;
  float edge2 = edge * edge;
  float rest = 0.34 + 0.05 * n.y + 0.61 * key + 0.13 * fill;
  rest = rest * (1.0 - 0.34 * edge2) + 0.16 * edge2 * edge2 * edge2 * abs(n.x);
  vec3 r = reflect(-v, n);
  // How far round the mirrored direction points: -1 left, 0 towards the eye, 1 right, on to 2 straight behind.
  float round_ = r.x * inversesqrt(r.x * r.x + r.z * r.z + 1e-6);
  round_ = r.z < 0.0 ? sign(round_) * (2.0 - abs(round_)) : round_;
  float tall = smoothstep(-0.68, -0.25, r.y) * (1.0 - smoothstep(0.68, 0.91, r.y));
  float lamps = tall * (lamp(round_, -0.87, 0.08, 0.17) + 0.45 * lamp(round_, 0.96, 0.04, 0.09));
  float ceiling = smoothstep(0.80, 0.97, r.y) * (0.55 + 0.45 * smoothstep(0.6, -0.6, r.x));
  float shine = vLook.y * lamps * (0.12 + 0.80 * edge2 * edge2 - 0.075 * edge);
  shine += smoothstep(0.6, 1.0, vLook.y) * ceiling * 0.30;
  vec3 light = surface(facing) * clamp(rest, 0.0, 1.08) * vLook.x + vec3(shine * vLook.x);
  colour = vec4(encoded(light), 1.0);
}`;

export const FLOOR_VERTEX = `#version 300 es
layout(location = 0) in vec2 corner;
uniform mat4 view;
uniform vec2 floorAt;     // height, half of the side
out vec2 vFloor;
void main() {
  vFloor = corner * floorAt.y;
  gl_Position = view * vec4(vFloor.x, floorAt.x, vFloor.y, 1.0);
}`;

export const FLOOR_FRAGMENT = `#version 300 es
precision highp float;
in vec2 vFloor;
uniform vec2 rest;        // radius of what stands there, how dark
out vec4 colour;
void main() {
  float out_ = max(0.0, length(vFloor) - rest.x) / rest.x;
  float near = exp(-out_ * 14.0) * 0.6 + exp(-out_ * 4.0) * 0.4;
  float fade = 1.0 - smoothstep(0.55, 0.80, out_);
  colour = vec4(0.0, 0.0, 0.0, rest.y * near * fade);
}`;
