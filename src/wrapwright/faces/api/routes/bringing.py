"""Files that people bring: pictures, fonts, profiles."""

from __future__ import annotations

from anyio import to_thread
from fastapi import APIRouter
from starlette.requests import Request

from wrapwright.faces.api.asking import QUIET, RAW, BenchAsked, Name, Sha256
from wrapwright.faces.api.incoming import MB, arriving
from wrapwright.jobs.kept.pictures import (
    FamilyKept,
    KeepFont,
    KeepPicture,
    ListFonts,
    ListPictures,
    RemovePicture,
    ShowPicture,
    keep_font,
    keep_picture,
    list_fonts,
    list_pictures,
    remove_picture,
    show_picture,
)
from wrapwright.jobs.kept.setups import KeepProfile, ProfileKept, keep_profile
from wrapwright.outside.store.records import FontKept, PictureKept

router = APIRouter(tags=["files"])


@router.put("/pictures/{name}", status_code=201, openapi_extra=RAW)
async def bring_picture(name: Name, request: Request, bench: BenchAsked) -> PictureKept:
    """Return the picture kept; its file is the body as it is. The same content twice is kept once."""
    async with arriving(request, name, bench.folders.data) as come:
        return await to_thread.run_sync(keep_picture, KeepPicture(come.name, come.file, move=True), bench, QUIET)


@router.get("/pictures")
def pictures(bench: BenchAsked) -> tuple[PictureKept, ...]:
    """Return all pictures, the newest first."""
    return list_pictures(ListPictures(), bench, QUIET)


@router.get("/pictures/{sha256}")
def picture(sha256: Sha256, bench: BenchAsked) -> PictureKept:
    """Return one picture."""
    return show_picture(ShowPicture(sha256), bench, QUIET)[0]


@router.delete("/pictures/{sha256}", status_code=204)
def no_picture(sha256: Sha256, bench: BenchAsked) -> None:
    """Remove a picture that no design uses."""
    remove_picture(RemovePicture(sha256), bench, QUIET)


@router.put("/fonts/{name}", status_code=201, openapi_extra=RAW)
async def bring_font(name: Name, request: Request, bench: BenchAsked) -> FontKept:
    """Return the font kept; its file is the body as it is, at most 64 MB."""
    async with arriving(request, name, bench.folders.data, biggest=64 * MB) as come:
        return await to_thread.run_sync(keep_font, KeepFont(come.name, come.file, move=True), bench, QUIET)


@router.get("/fonts")
def fonts(bench: BenchAsked) -> tuple[FamilyKept, ...]:
    """Return the families that texts may be set in, by name."""
    return list_fonts(ListFonts(), bench, QUIET)


@router.put("/profiles/{name}", status_code=201, openapi_extra=RAW)
async def bring_profile(name: Name, request: Request, bench: BenchAsked) -> ProfileKept:
    """Return the ICC profile kept; its file is the body as it is, at most 64 MB."""
    async with arriving(request, name, bench.folders.data, biggest=64 * MB) as come:
        return await to_thread.run_sync(keep_profile, KeepProfile(come.name, come.file, move=True), bench, QUIET)
