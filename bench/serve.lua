-- serve.lua - for wrk: the addresses after "--", in turn, as a browser asks for
-- them; prints one line.  With WARM=1 it counts the pages still being computed.
local threads = {}
local path, at = {}, 0
coming = 0

function setup(thread)
	table.insert(threads, thread)
end

function init(args)
	for _, address in ipairs(args) do
		table.insert(path, address)
	end
	wrk.headers["Accept-Encoding"] = "gzip"
end

function request()
	at = at % #path + 1
	return wrk.format("GET", path[at])
end

if os.getenv("WARM") then
	function response(status)
		if status == 202 then
			coming = coming + 1
		end
	end
end

function done(summary, latency)
	local still = 0
	local errors = summary.errors
	for _, thread in ipairs(threads) do
		still = still + thread:get("coming")
	end
	io.write(string.format(
		"RESULT %d %.0f %.2f %.2f %d %d %.0f\n", summary.requests,
		summary.requests / summary.duration * 1e6,
		latency:percentile(50) / 1000, latency:percentile(99) / 1000,
		still, errors.status + errors.connect + errors.read
			+ errors.write + errors.timeout,
		summary.bytes / summary.requests))
end
