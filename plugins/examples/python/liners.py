#!/usr/bin/env python3
"""A catalogue plugin in Python, with no generated code: it writes the few protobuf fields it needs by hand.

It needs the grpc package (Debian: python3-grpcio), and is configured with PlainSocket since it has no certificates.
Print nothing to stdout but the handshake, and log to stderr.
"""
import hashlib
import os
import signal
import struct
import sys
import threading
from concurrent import futures

import grpc

# Invented data: number, description, m² on hand, material (1 is EPDM), thickness in mm, kg/m², price a m², roll width in m.
LINERS = [
    ("PY-075", "EPDM lining 0.75 mm", 240, 1, 0.75, 0.95, 6.20, 12.2),
    ("PY-100", "EPDM lining 1.0 mm", 0, 1, 1.0, 1.25, 8.40, 15.25),
    ("PY-U", "protective fleece 300 g/m²", 900, 5, 2.5, 0.3, 1.60, 2.0),
]


def varint(n):
    return bytes([n]) if n < 128 else bytes([n & 127 | 128]) + varint(n >> 7)


def field(number, value):
    """One protobuf field: a number, a whole number, a text, or a message that is written already."""
    if isinstance(value, float):
        return varint(number << 3 | 1) + struct.pack("<d", value)
    if isinstance(value, int):
        return varint(number << 3) + varint(value)
    raw = value.encode() if isinstance(value, str) else value
    return varint(number << 3 | 2) + varint(len(raw)) + raw


def item(number, description, on_hand, material, thickness, mass, price, width):
    liner = field(1, material) + field(2, thickness) + field(3, mass) + field(4, width) + field(5, price)
    return field(1, number) + field(2, description) + field(4, on_hand) + field(14, liner)


def pages(request, context):
    size = sum((b & 127) << 7 * i for i, b in enumerate(request[1:])) or 250  # page_size, the one field of the request
    return (b"".join(ITEMS[i:i + size]) for i in range(0, len(ITEMS), size))


ITEMS = [field(1, item(*liner)) for liner in LINERS]
ABOUT = (field(1, "Linings (invented)") + field(2, hashlib.sha256(b"".join(ITEMS)).hexdigest()[:16]) + field(3, "GBP")
         + field(4, "Invented data for demonstration") + field(5, 5))  # kind 5 is a liner


def main():
    if os.environ.get("PONDWRIGHT_CATALOGUE_PLUGIN") != "9f0c5b1e-catalogue":
        sys.exit("This is a catalogue plugin: the engine starts it.")
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    stop = threading.Event()
    unary, stream = grpc.unary_unary_rpc_method_handler, grpc.unary_stream_rpc_method_handler
    server = grpc.server(futures.ThreadPoolExecutor(4))
    server.add_generic_rpc_handlers((
        grpc.method_handlers_generic_handler("pondwright.catalogue.v1.MerchantCatalogueService", {
            "Describe": unary(lambda request, context: ABOUT),
            "StreamItems": stream(pages)}),
        grpc.method_handlers_generic_handler("grpc.health.v1.Health", {"Check": unary(lambda request, context: field(1, 1))}),
        grpc.method_handlers_generic_handler("plugin.GRPCController", {"Shutdown": unary(lambda request, context: (stop.set(), b"")[1])}),
    ))
    socket = os.path.join(os.environ["PLUGIN_UNIX_SOCKET_DIR"], "s")
    server.add_insecure_port("unix:" + socket)
    server.start()
    print("1|1|unix|" + socket + "|grpc|", flush=True)  # core and catalogue protocol, both version 1
    parent = os.getppid()
    while not stop.wait(1) and os.getppid() == parent:
        pass
    server.stop(0.2).wait()


if __name__ == "__main__":
    main()
