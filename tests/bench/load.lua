-- For wrk: posts drains under ids of their own, or gets the path of the address over and over, and
-- prints what became of it as one line of JSON. The environment says what is sent:
--   BENCH_TOKEN   the token of a session
--   BENCH_DRAINS  the time at which drains occurred, RFC 3339; unset: GETs
--   BENCH_RUN     a number below 4096, another one for each run against one book
local token = os.getenv("BENCH_TOKEN")
local occurred_at = os.getenv("BENCH_DRAINS")
local run = tonumber(os.getenv("BENCH_RUN"))
local started_ms = os.time() * 1000
local number = 0
local before, after

-- A UUID of version 7 (RFC 9562): the time, which goes on by 1 ms every 16 requests, then the run
-- and the number of the request in the place of random bits.
local function next_id()
  number = number + 1
  local ms = started_ms + math.floor(number / 16)
  return string.format("%08x-%04x-7%03x-8000-%012x",
    math.floor(ms / 65536), ms % 65536, run, number)
end

function init()
  local headers = { ["Authorization"] = "Bearer " .. token }
  if not occurred_at then
    before = wrk.format("GET", wrk.path, headers)
    return
  end
  headers["Content-Type"] = "application/json"
  local body = string.format('{"id":"%036d","kind":"oil-drained","occurred_at":"%s",' ..
    '"fields":{"container":"tank","volume_ml":62.5}}', 0, occurred_at)
  local whole = wrk.format("POST", "/api/v1/entries", headers, body)
  local start = whole:find(string.rep("0", 36), 1, true)
  before, after = whole:sub(1, start - 1), whole:sub(start + 36)
end

function request()
  if not occurred_at then return before end
  return before .. next_id() .. after
end

function done(summary, latency)
  local errors = summary.errors
  io.write(string.format('{"requests":%d,"seconds":%.6f,"not_2xx":%d,"broken":%d,' ..
    '"latency_median_ms":%.3f,"latency_p99_ms":%.3f}\n',
    summary.requests, summary.duration / 1e6, errors.status,
    errors.connect + errors.read + errors.write + errors.timeout,
    latency:percentile(50) / 1e3, latency:percentile(99) / 1e3))
end
