"""The routes, one module a thing they are about; handlers only read the request and call the job."""
